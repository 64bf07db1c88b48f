-- expect: a quote is opened and not closed in its line
return { name = "A,
 overflow_level = 1 }
