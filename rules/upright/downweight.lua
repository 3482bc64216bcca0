-- Downweight of an upright, on samples, with the upweight in one visit. Springs work in it; lead is seldom the answer.
return step {
  id = "downweight", title = "Downweight", stage = "weigh", unit = "g", scope = "every", need = "samples",
  plain = "How heavy the keys feel",
  ask = "Dampers lifted by the pedal. Weight at the usual point at the key front. Weigh before let-off is met.",
  why = "What the player lifts: leverage, mass, springs and friction together.",
  target = at_most(60, 52),              -- the aim is mean weight and friction together; light is no fault by itself
  resolution = 1, gauge = 1,
  pair = "upweight",
  high_todo = "Cure friction and weigh again, then look at the butt spring.",
  method = "gram weights, dampers lifted",
  unsourced = true,
}
