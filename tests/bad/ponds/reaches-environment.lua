-- expect: there is no unit 'os'
return _ENV.os.execute("true")
