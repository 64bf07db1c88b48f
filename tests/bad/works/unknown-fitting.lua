-- expect: pipes[1].fittings '90 elbo' is none of its names: did you mean '90 elbow
return { basin = { length = 4, width = 3, depth = 1.2 }, overflow_level = 1.1,
  pipes = { { to = "bed", size = "2", length = 8, fittings = { ["90 elbo"] = 2 } } } }
