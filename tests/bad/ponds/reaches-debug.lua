-- expect: global 'debug'
return debug.getregistry()
