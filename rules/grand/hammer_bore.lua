-- Hammer bore: string height less the height of the hammer centre, so that the hammer stands square at the string.
return step {
  id = "hammer_bore", title = "Hammer bore", stage = "survey", unit = "mm", scope = "sections", need = "optional",
  plain = "Measured once, before any work",
  ask = "Measure from the middle of the shank to the crown of the hammer.",
  why = "Bored too short, the shank passes level before it strikes; too long, it strikes from below.",
  target = range(44, 58, 50),
  resolution = 0.5, gauge = 0.5,
  low_todo = "Compare with string height less centre height. Filed hammers are short: say so before regulating.",
  high_todo = "Compare with string height less centre height. These may be another model's hammers.",
  unsourced = true, source = "list-2004-string-height: 48 mm on one model; common-practice: the band",
}
