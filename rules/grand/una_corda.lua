-- Una corda: how far the action shifts. Clear or graze is the book's choice.
return step {
  id = "una_corda", title = "Una corda", stage = "dampers", kind = "judged", scope = "once",
  plain = "Pedals",
  ask = by_choice { "una_corda",
    clear = "Press the shift pedal. All three-string hammers just leave their left string, together. Let go: " ..
      "the action comes home.",
    graze = "Press the shift pedal. All three-string hammers still brush their left string, alike. Let go: " ..
      "the action comes home.",
  },
  why = "Clear or graze is the shop's choice. A shift that differs from note to note is nobody's.",
  faults = by_choice { "una_corda",
    clear = {
      { "short", means = "left strings still struck", fix = { { "shift_stop", "further" } } },
      { "far", means = "hammers touch the next note", fix = { { "shift_stop", "shorter" } } },
      { "no_return", means = "does not come home",
        todo = "Free the frame, look at the shift spring and the hold-downs." },
      { "ragged", means = "hammers leave the string at different points", todo = "Go back to hammer spacing." },
    },
    graze = {
      { "short", means = "left strings struck in full", fix = { { "shift_stop", "further" } } },
      { "far", means = "left strings missed", fix = { { "shift_stop", "shorter" } } },
      { "no_return", means = "does not come home",
        todo = "Free the frame, look at the shift spring and the hold-downs." },
      { "ragged", means = "some hammers brush, others miss", todo = "Go back to hammer spacing." },
    },
  },
  source = "maker-shift-guide; list-1995-shift-half; list-1996-pedals",
}
