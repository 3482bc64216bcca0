-- Downweight of an upright, on samples. Springs work in it, so lead is seldom the answer.
return step {
  id = "downweight", title = "Downweight", stage = "weigh", unit = "g", scope = "every", need = "samples",
  plain = "How heavy the keys feel",
  ask = "Dampers lifted by the pedal. Weight at the usual point at the key front. Weigh before let-off is met.",
  why = "What the player lifts: leverage, mass, springs and friction together.",
  target = range(45, 60, 52),
  resolution = 1, gauge = 1,
  method = "gram weights, dampers lifted",
  unsourced = true,
}
