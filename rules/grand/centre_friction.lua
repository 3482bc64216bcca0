-- Friction of the hammer centre in grams, where a shop pins by gauge.
return step {
  id = "centre_friction", title = "Hammer centre, grams", stage = "survey", unit = "g", scope = "every",
  need = "optional",
  plain = "How heavy the keys feel",
  ask = "Hammer off its rail. Draw the shank round its centre with a gram gauge, 23 mm from the pin.",
  why = "Friction in the centres weighs like hammers and wanders with the seasons.",
  target = range(2, 5, 3.5),
  resolution = 0.5, gauge = 0.5, even = 1, breaks = false,
  low_todo = "Repin with the next size of pin.",
  high_todo = "Free the centre, or repin it.",
  method = "gram gauge at 23 mm",
  caution = "A reamed or thin bushing has little cloth and glue left: go up one pin size at a time.",
  source = "parts-2023-flanges: 2 to 5 g at 23 mm",
}
