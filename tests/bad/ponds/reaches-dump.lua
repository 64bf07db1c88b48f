-- expect: global 'string'
return load(string.dump(function() end))
