-- Cases that do not come out as they say (readings invented).
return tests "tiny" {
  { "blow", "A4", reads = 48, want = "pass", source = "a slip" },
  { "blow", "A4", reads = 48, want = "fail", why = "high", fix = { "capstan", "raise", 2 }, source = "a slip" },
  { "blow", "A4", reads = 48, want = "fail", why = "high", fix = { "capstan", "lower" }, source = "a slip" },
  { "blow", "A4", reads = 45, want = "pass", fix = { "capstan", "raise" }, source = "a slip" },
  { "blow", "A4", reads = '1 25/32"', want = "pass", source = "arithmetic: 45.24 mm" },
  { "blow", "A4", reads = "45 mm", want = "pass", source = "arithmetic" },
}
