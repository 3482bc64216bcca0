-- The soft play test: it finds what firm test blows hide.
return step {
  id = "play_soft", title = "Play softly", stage = "finish", kind = "judged", scope = "every",
  plain = "Playing each note softly and firmly",
  ask = "Play each note as softly as it will speak, then a slow chromatic run.",
  why = "Sticking, blocking and uneven let-off hide under firm blows.",
  faults = {
    { "silent", means = "does not speak", todo = "Look at let-off, aftertouch and friction." },
    { "double", means = "strikes twice", todo = "Look at lost motion, checking and the springs." },
    { "sticks", means = "slow to come back", todo = "Look at the key and centres. Try it with the pedal down too." },
    { "stands_out", means = "feels or sounds unlike its neighbours",
      todo = "Open a query on this note. Look until the cause is found." },
  },
  source = "list-1996-soft-play",
}
