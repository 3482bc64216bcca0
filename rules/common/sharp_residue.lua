-- Sharp residue: what still stands above the naturals when the sharp is down.
return step {
  id = "sharp_residue", title = "Sharp above naturals when down", stage = "refine", kind = "derived", unit = "mm",
  scope = "sharps",
  plain = "Keys: level, evenly spaced, free to move",
  ask = "Nothing to read: sharp height less the dip of the sharp.",
  formula = "sharp_height - key_dip",
  target = range(1.5, 2.6, 2),
  resolution = 0.1,
  fix = { "front_punching" },
  why = "A sharp that goes down too far lets the finger strike the naturals beside it.",
  source = "page-dealer-sharps; page-service; arithmetic: 12 - 10, 12.7 - 10.67; common-practice: limits",
}
