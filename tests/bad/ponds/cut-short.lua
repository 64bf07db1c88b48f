-- expect: the file ends in the middle: was all of it copied?
return { basin = { shape = "rectangle", length =
