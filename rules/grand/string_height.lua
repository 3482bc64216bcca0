-- String height above the keybed, at section ends. The strings are where every other height is counted from.
return step {
  id = "string_height", title = "String height", stage = "survey", unit = "mm", scope = "sections", need = "optional",
  plain = "Measured once, before any work",
  ask = "Action out. Measure from keybed to the underside of the string at the strike line.",
  why = "Bore, shank height and blow all follow from it. Sister pianos differ by millimetres.",
  target = range(180, 205, 192),
  resolution = 0.5, gauge = 0.5,
  low_todo = "Measure again from the keybed. If it is so, write it down: no screw changes it.",
  high_todo = "Measure again from the keybed. If it is so, write it down: no screw changes it.",
  method = "rule or gauge on the keybed",
  unsourced = true, source = "list-2004-string-height: 188 to 194 mm on one make",
}
