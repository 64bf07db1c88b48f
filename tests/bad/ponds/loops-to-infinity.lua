-- expect: runs too long for a description
for i = 1, 1e308 do end
