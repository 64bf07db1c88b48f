-- expect: there is no unit 'package'
return package.loadlib("libc.so.6", "system")
