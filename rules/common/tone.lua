-- Tone and voicing: the last judgement, and outside the numbers of this book.
return step {
  id = "tone", title = "Tone", stage = "finish", kind = "judged", scope = "every", need = "optional",
  plain = "Playing each note softly and firmly",
  ask = "Play a slow scale softly, then firmly. Each note speaks like its neighbours.",
  why = "An uneven regulation sounds like uneven hammers, so hammers are voiced last.",
  faults = {
    { "harsh", means = "harder or brighter than its neighbours",
      todo = "First regulation and string fit, then the hammer's felt." },
    { "dull", means = "softer or duller than its neighbours",
      todo = "First regulation and string fit, then the hammer's felt." },
    { "uneven", means = "changes with the pedal or between soft and loud",
      todo = "Fit the hammer to its strings again, then voice." },
  },
  unsourced = true, source = "common-practice",
}
