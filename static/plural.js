// Words that depend on a number, in the page's language. The server gives them for a few numbers;
// of these, the one with the same kind of plural (CLDR) lends its words to any other.
const rules = new Intl.PluralRules(document.documentElement.lang);

export function counted(json, number) {
  const words = JSON.parse(json);
  const like = Object.keys(words).find((n) => rules.select(Number(n)) === rules.select(number));
  return (words[like] ?? Object.values(words).at(-1)).replace("{n}", number);
}
