-- expect: tarn new NAME.lua writes one
name,value
length,12
