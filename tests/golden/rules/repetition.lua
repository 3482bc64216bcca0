return step {
  id = "repetition", title = "Repetition", kind = "judged", stage = "set",
  plain = "How quickly a note can be repeated",
  ask = "Play it fast.", why = "The spring lifts the hammer.", unsourced = true,
  faults = {
    { "weak", means = "the hammer does not rise", fix = { { "repetition_spring", "stronger" } } },
    { "noisy", means = "the spring squeaks", todo = "Clean the slot and graphite it." },
  },
}
