-- Spring and loop: where a butt spring hooks into a cord on its flange.
return step {
  id = "spring_loops", title = "Spring and loop", stage = "bench", kind = "judged", scope = "every", need = "optional",
  plain = "How quickly a note can be repeated",
  ask = "Where the flange has a loop: the cord is whole, and the spring hooks into its middle.",
  why = "A torn loop leaves the hammer without its spring, and the note does not repeat.",
  caution = "Springs: mind your eyes.",
  faults = {
    { "torn", means = "cord torn or perished", todo = "Renew the cord. One that has perished is seldom alone." },
    { "unhooked", means = "spring beside its loop", todo = "Hook it in; look whether the cord has stretched." },
  },
  unsourced = true,
}
