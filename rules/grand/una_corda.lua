-- Una corda: how far the action shifts. Default school: the left string is just cleared.
return step {
  id = "una_corda", title = "Una corda", stage = "dampers", kind = "judged", scope = "once",
  ask = "Press the shift pedal. All three-string hammers just leave their left string, together. Let go: " ..
    "the action comes home.",
  why = "Clear or graze is the shop's choice. A shift that differs from note to note is nobody's.",
  faults = {
    { "short", means = "left strings still struck", fix = { { "shift_stop", "further" } } },
    { "far", means = "hammers touch the next note", fix = { { "shift_stop", "shorter" } } },
    { "no_return", means = "does not come home",
      todo = "Free the frame, look at the shift spring and the hold-downs." },
    { "ragged", means = "hammers leave the string at different points", todo = "Go back to hammer spacing." },
  },
  source = "docs/numbers.md#una_corda",
}
