-- expect: global 'os'
return _ENV.os.execute("true")
