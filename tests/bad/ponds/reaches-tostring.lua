-- expect: global 'tostring'
return { name = tostring(_ENV) }
