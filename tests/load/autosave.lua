-- What 50 couples send while they type, for wrk: after every "open" of a step nine drafts of it.
-- Each line of the file COUPLES: path, cookies, body of a draft; tabs between.
local couples, turn = {}, 0
local every = tonumber(os.getenv("EVERY")) -- milliseconds between what one couple sends
threads = {}

function setup(thread)
  table.insert(threads, thread)
  thread:set("number", #threads)
end

function init(args)
  for line in io.lines(os.getenv("COUPLES")) do
    local path, cookies, body = line:match("^(.-)\t(.-)\t(.*)$")
    table.insert(couples, { path = path, cookies = cookies, body = body, sent = 0 })
  end
  math.randomseed(number)
  refused = 0
end

function delay()
  return math.random(every / 2, every * 3 / 2)
end

function request() -- two threads: one takes the even couples, one the odd
  turn = turn + 1
  local couple = couples[(turn * 2 + number) % #couples + 1]
  couple.sent = couple.sent + 1
  if couple.path == "/bare" or couple.sent % 10 == 1 then
    return wrk.format("GET", couple.path, { Cookie = couple.cookies })
  end
  local body = couple.body:gsub("WORDS", "typed+" .. couple.sent .. "+by+" .. number)
  return wrk.format("POST", couple.path, {
    Cookie = couple.cookies, ["Content-Type"] = "application/x-www-form-urlencoded",
  }, body)
end

function response(status)
  if status ~= 200 then refused = refused + 1 end
end

function done(summary, latency)
  local failed = summary.errors.connect + summary.errors.read + summary.errors.write
  failed = failed + summary.errors.timeout
  for _, thread in ipairs(threads) do failed = failed + thread:get("refused") end
  print(string.format('{"sent": %d, "errors": %d, "p50": %.1f, "p95": %.1f, "worst": %.1f}',
    summary.requests, failed, latency:percentile(50) / 1000, latency:percentile(95) / 1000,
    latency.max / 1000))
end
