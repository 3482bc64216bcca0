-- Jack springs: what brings each jack home under its butt.
return step {
  id = "jack_spring_feel", title = "Jack springs", stage = "bench", kind = "judged", scope = "every",
  need = "optional",
  plain = "How quickly a note can be repeated",
  ask = "Press the jack's toe and let go slowly. Its spring brings it all the way home, like its neighbours.",
  why = "A jack without its spring comes home late, or not at all.",
  faults = {
    { "weak", means = "comes home slowly", fix = { { "jack_spring", "stronger" } },
      todo = "Try the jack's centre first." },
    { "strong", means = "heavier to press than its neighbours", fix = { { "jack_spring", "weaker" } } },
    { "off", means = "spring out of its place, or broken", todo = "Put it back, or renew it." },
  },
  unsourced = true,
}
