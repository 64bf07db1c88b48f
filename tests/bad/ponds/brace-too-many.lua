-- expect: :2: nothing may follow the } that ends the description
return { basin = { shape = "ellipse" } } }
