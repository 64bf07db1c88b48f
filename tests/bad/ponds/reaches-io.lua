-- expect: global 'io'
return { name = io.open("/etc/passwd"):read("a") }
