// The little Markdown of a card: bold, code, links, and a backslash before what is none of it. Nothing becomes markup but these.
const part = /\\([\\`*_{}[\]<>#|~&@!$+.=)(-])|\*\*((?:\\.|[^\\*])+)\*\*|`([^`]*)`|\[((?:\\.|[^\\\]])+)\]\((https:\/\/[^\s)]+)\)/g;

const plain = (text: string): string => text.replace(/\\([^\p{L}\p{N}\s])/gu, "$1");

const element = (name: string, text: string): HTMLElement => {
  const made = document.createElement(name);
  made.textContent = text;
  return made;
};

const line = (text: string): HTMLElement => {
  const made = document.createElement("div");
  let at = 0;
  for (const match of text.matchAll(part)) {
    made.append(text.slice(at, match.index));
    at = match.index + match[0].length;
    const [, escaped, bold, code, words] = match;
    if (escaped !== undefined) made.append(escaped);
    else if (bold !== undefined) made.append(element("strong", plain(bold)));
    else if (code !== undefined) made.append(element("code", code));
    // A page of a rule lies elsewhere, and nothing here leads away.
    else made.append(plain(words ?? ""));
  }
  made.append(text.slice(at));
  return made;
};

/** A card as elements. */
export const card = (lines: readonly string[]): HTMLElement => {
  const made = document.createElement("div");
  made.className = "card";
  made.append(...lines.map(line));
  return made;
};
