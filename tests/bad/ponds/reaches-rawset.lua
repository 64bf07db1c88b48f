-- expect: global 'rawset'
rawset(_ENV, "ft", 1e9)
