-- The damper tray: free, quiet, and brought home by its own weight and spring.
return step {
  id = "tray_return", title = "Damper tray comes home", stage = "dampers", kind = "judged", scope = "once",
  need = "optional",
  plain = "Pedals",
  ask = "Press and let go of the damper pedal, slowly and fast. The tray comes home at once, without a knock.",
  why = "A tray that lags holds dampers off their strings.",
  caution = "Tray springs are strong: mind eyes and fingers.",
  faults = {
    { "slow", means = "comes home late, or stays a little up",
      todo = "Free its centres, then the spring, then the rods." },
    { "knocks", means = "knocks or squeaks",
      todo = "Renew felt or leather at the knock; a dry lubricant at the squeak." },
  },
  unsourced = true, source = "common-practice",
}
