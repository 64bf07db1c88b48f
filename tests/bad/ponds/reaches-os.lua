-- expect: there is no unit 'os'
os.execute("true")
return {}
