-- expect: there is no unit 'debug'
return debug.getregistry()
