-- Key spacing: even gaps, square keys. The pitch of 23.5 mm is a design figure, so this is judged.
return step {
  id = "key_spacing", title = "Key spacing", stage = "prepare", kind = "judged", scope = "every",
  plain = "Keys: level, evenly spaced, free to move",
  ask = "Look along the key fronts. Gaps are even and each key stands square.",
  why = "Keys that touch rub. A leaning key reads falsely for level and dip.",
  faults = {
    { "left", means = "stands to the left", todo = "Bend the front or balance pin to the right with a spacing tool." },
    { "right", means = "stands to the right", todo = "Bend the front or balance pin to the left with a spacing tool." },
    { "leans", means = "top is not level from side to side", todo = "Square the key at the balance pin." },
  },
  source = "page-2006-key-widths",
}
