-- expect: there is no unit 'tostring'
return { name = tostring(_ENV) }
