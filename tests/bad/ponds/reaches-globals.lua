-- expect: there is no unit '_G'
return _G.os.execute("true")
