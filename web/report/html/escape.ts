const signs: Readonly<Record<string, string>> = {
  '&': '&amp;',
  '<': '&lt;',
  '>': '&gt;',
  '"': '&quot;',
  "'": '&#39;',
}

/**
 * Text as it stands in HTML, SVG and XML, between tags and in attributes. Characters that XML 1.0 does not know
 * (2.2) are named, never dropped.
 */
export function escapeMarkup(text: string): string {
  return text
    .replace(
      // biome-ignore lint/suspicious/noControlCharactersInRegex: it is they that are looked for.
      /[\u0000-\u0008\u000b\u000c\u000e-\u001f\ufffe\uffff]/g,
      (character) => `[${codePointName(character)}]`,
    )
    .replace(/[\ud800-\udbff](?![\udc00-\udfff])|(?<![\ud800-\udbff])[\udc00-\udfff]/g, '\ufffd')
    .replace(/[&<>"']/g, (character) => signs[character] ?? character)
}

/** A character by its name in Unicode's own notation: 'U+4E2D'. */
export const codePointName = (character: string): string =>
  `U+${(character.codePointAt(0) ?? 0).toString(16).toUpperCase().padStart(4, '0')}`
