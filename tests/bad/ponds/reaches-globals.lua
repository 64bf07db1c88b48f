-- expect: global '_G'
return _G.os.execute("true")
