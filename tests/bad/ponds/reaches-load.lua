-- expect: attempt to call a nil value (global 'load')
return load("return {}")()
