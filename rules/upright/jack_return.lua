-- Jack return: an upright's repetition.
return step {
  id = "jack_return", title = "Jack return", stage = "refine", kind = "judged", scope = "every",
  plain = "How quickly a note can be repeated",
  ask = "Catch the hammer, then let the key up slowly. The jack snaps under the butt before the key is up.",
  why = "A jack that comes home late loses the next blow.",
  faults = {
    { "late", means = "jack comes home late",
      todo = "See that lost motion is not all gone, then look at jack spring, centre and butt leather." },
    { "hangs", means = "jack stays out", fix = { { "jack_spring", "stronger" } },
      todo = "First free the jack's centre." },
  },
  unsourced = true,
}
