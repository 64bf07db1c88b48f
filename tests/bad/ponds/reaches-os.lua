-- expect: attempt to index a nil value (global 'os')
os.execute("true")
return {}
