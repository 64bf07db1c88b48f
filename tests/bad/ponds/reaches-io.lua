-- expect: there is no unit 'io'
return { name = io.open("/etc/passwd"):read("a") }
