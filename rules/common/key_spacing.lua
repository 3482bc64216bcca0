-- Key spacing: even gaps, square keys. The pitch of 23.5 mm is a design figure, so this is judged.
return step {
  id = "key_spacing", title = "Key spacing", stage = "prepare", kind = "judged", scope = "every",
  plain = "Keys: level, evenly spaced, free to move",
  ask = "Look along the key fronts. Gaps are even and each key stands square.",
  why = "Keys that touch rub. A leaning key reads falsely for level and dip.",
  faults = {
    { "left", means = "stands to the left", fix = { { "pin_bend", "to the right" } } },
    { "right", means = "stands to the right", fix = { { "pin_bend", "to the left" } } },
    { "leans_left", means = "its top leans to the left", fix = { { "pin_bend", "to the right" } },
      todo = "At the balance pin." },
    { "leans_right", means = "its top leans to the right", fix = { { "pin_bend", "to the left" } },
      todo = "At the balance pin." },
    { "leans", means = "top is not level from side to side", todo = "Square the key at the balance pin." },
  },
  source = "page-2006-key-widths",
}
