-- expect: there is no unit 'load'
return load(string.dump(function() end))
