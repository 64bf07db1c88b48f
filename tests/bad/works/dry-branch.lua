-- expect: the pump cannot lift to the bed
return { basin = { length = 4, width = 3, depth = 1.2 }, overflow_level = 1.1,
  pump = { max_head = 10 * ft, label_flow = 3000 * gph },
  pipes = { { to = "bed", size = "1.5", length = 8, lift = 9 * ft },
    { to = "pond", size = "1", length = 3, orifice = 0.5 * inch, orifices = 8 } } }
