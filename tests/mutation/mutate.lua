-- mutate.lua - one small wrong thing in a C file at a time.
--
--   mutate.lua FILE             lists the mutants: number, line, what was changed
--   mutate.lua FILE NUMBER      prints the file with that one
--
-- Changed are: < <= > >= == !=, binary + and -, += and -=, && and ||, numbers in comparisons and
-- #defines (one more), and a return inside a function is dropped.  Comments, texts and other lines of
-- the preprocessor are left alone.
local path, wanted = arg[1], tonumber(arg[2] or "")
local file = assert(io.open(path, "rb"))
local text = file:read("a")
file:close()

-- Blanks in place of comments and texts, so that places stay the same.
local function blank(s)
  return (s:gsub("[^\n]", " "))
end
local plain = {}
local at = 1
while at <= #text do
  local c2, c = text:sub(at, at + 1), text:sub(at, at)
  local stop
  if c2 == "/*" then
    stop = select(2, text:find("*/", at + 2, true)) or #text
  elseif c2 == "//" then
    stop = (text:find("\n", at, true) or #text + 1) - 1
  elseif c == '"' or c == "'" then
    stop = at + 1
    while stop <= #text and text:sub(stop, stop) ~= c do
      stop = stop + (text:sub(stop, stop) == "\\" and 2 or 1)
    end
  end
  if stop then
    plain[#plain + 1] = blank(text:sub(at, stop))
    at = stop + 1
  else
    plain[#plain + 1] = c
    at = at + 1
  end
end
plain = table.concat(plain)

local mutants = {} -- { from, to, by }
local function add(from, to, by, what)
  mutants[#mutants + 1] = { from = from, to = to, by = by, what = what }
end

local swaps = {
  ["<="] = "<", [">="] = ">", ["=="] = "!=", ["!="] = "==", ["&&"] = "||", ["||"] = "&&",
  ["+="] = "-=", ["-="] = "+=",
}
local singles = { ["<"] = "<=", [">"] = ">=", ["+"] = "-", ["-"] = "+" }
local left_alone = { ["<<"] = true, [">>"] = true, ["->"] = true, ["++"] = true, ["--"] = true }

local function is_binary(place)
  local before = plain:sub(1, place - 1):match("(%S)%s*$")
  local word = plain:sub(1, place - 1):match("([%a_]+)%s*$")
  return before and before:find("[%w_%)%]]") and word ~= "return" and word ~= "case"
end

local offset = 1
local lines = {}
for line in (plain .. "\n"):gmatch("(.-)\n") do
  lines[#lines + 1] = { text = line, at = offset }
  offset = offset + #line + 1
end

local function mutate_operators(line)
  local i = 1
  while i <= #line.text do
    local two, one = line.text:sub(i, i + 1), line.text:sub(i, i)
    local from = line.at + i - 1
    if left_alone[two] then
      i = i + 2
    elseif swaps[two] then
      add(from, from + 1, swaps[two], two .. " -> " .. swaps[two])
      i = i + 2
    elseif singles[one] and (one == "<" or one == ">" or is_binary(from)) then
      add(from, from, singles[one], one .. " -> " .. singles[one])
      i = i + 1
    else
      i = i + 1
    end
  end
end

local function mutate_numbers(line)
  for from, digits, to in line.text:gmatch("%f[%w_]()(%d+)()%f[^%w_.]") do
    local more = tostring(tonumber(digits) + 1)
    local before = line.text:sub(1, from - 1):match("(.?)%s*$")
    if before ~= "." and before ~= "[" then
      add(line.at + from - 1, line.at + to - 2, more, digits .. " -> " .. more)
    end
  end
end

for i, line in ipairs(lines) do
  local is_define = line.text:match("^%s*#%s*define%s")
  if is_define then
    mutate_numbers(line)
  elseif not line.text:match("^%s*#") then
    mutate_operators(line)
    if line.text:find("[<>=!]=") or line.text:find("%s[<>]%s") then
      mutate_numbers(line)
    end
    -- The last statement of a function must stay, or the compiler does the killing.
    local from, to = line.text:find("return[^;]*;")
    local next_line = lines[i + 1] and lines[i + 1].text or ""
    if from and line.text:sub(1, from - 1):match("^%s*$") and not next_line:match("^}") then
      add(line.at + from - 1, line.at + to - 1, ";", "dropped " .. line.text:sub(from, to))
    end
  end
end

local function line_of(place)
  return select(2, text:sub(1, place):gsub("\n", "")) + 1
end
if wanted then
  local m = assert(mutants[wanted], "there is no such mutant")
  io.write(text:sub(1, m.from - 1), m.by, text:sub(m.to + 1))
else
  for i, m in ipairs(mutants) do
    print(i .. "\t" .. line_of(m.from) .. "\t" .. m.what)
  end
end
