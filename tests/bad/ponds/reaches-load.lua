-- expect: there is no unit 'load'
return load("return {}")()
