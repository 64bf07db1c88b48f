-- expect: has a key that is neither a name nor a number
return { [{}] = 1 }
