-- SPDX-License-Identifier: MIT
return {
  scenarios = { { name = "warm", weather = { temperature = 2 } } },
  inputs = { { field = "bed.area", times = { 0.5, 2 } }, { field = "rain", low = 0.8, high = 1.2 } },
  samples = 4, sensitivity = 8,
  tank = { roof = 30, capacities = { 0.1, 1 }, target = 0.5 },
  budget = { unit = 0.62, adjustment = 0.55, plant_factor = 1 },
}
