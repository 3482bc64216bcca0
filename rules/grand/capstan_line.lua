-- The capstan's line: at half stroke its contact lies on the line from balance pin to whippen centre.
return step {
  id = "capstan_line", title = "Capstan on its line", stage = "survey", kind = "judged", scope = "sections",
  need = "optional",
  plain = "Measured once, before any work",
  ask = "Hold a sample key at half its travel. Sight along a thread from balance pin to whippen centre: the " ..
    "capstan meets the cushion on it.",
  why = "Off that line the capstan slides under its cushion: friction that no oil cures.",
  faults = {
    { "above", means = "the contact lies above the line", todo = "Note it for the next rebuild: a thicker cushion, " ..
      "so that the capstan stands lower." },
    { "below", means = "the contact lies below the line", todo = "Note it for the next rebuild: a thinner cushion, " ..
      "so that the capstan stands higher." },
    { "off_line", means = "capstans are not in one straight line", todo = "Measure the arm of each sample; the " ..
      "ratios differ as the arms do." },
  },
  source = "list-1999-capstan-line; geometry",
}
