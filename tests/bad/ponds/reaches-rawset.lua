-- expect: there is no unit 'rawset'
rawset(_ENV, "ft", 1e9)
