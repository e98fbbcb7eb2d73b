import { XMLBuilder } from 'fast-xml-parser'

/** Elements in the order in which they stand; a list is an element that repeats, `@_` begins an attribute's name. */
export interface XmlElements {
  readonly [name: string]: XmlContent
}
type XmlContent = string | XmlElements | readonly (string | XmlElements)[] | undefined

const builder = new XMLBuilder({
  ignoreAttributes: false,
  format: true,
  suppressEmptyNode: true,
})

/** A document as text: UTF-8, what XML 1.0 has no character for replaced, elements that are undefined left out. */
export const toXmlDocument = (root: XmlElements): string =>
  `<?xml version="1.0" encoding="UTF-8"?>\n${builder.build(withoutUnknownCharacters(root))}`

// XML 1.0, production 2 (Char): everything else, lone surrogates among it.
const noCharacter = /[^\t\n\r\u0020-\uD7FF\uE000-\uFFFD\u{10000}-\u{10FFFF}]/gu

function withoutUnknownCharacters(content: XmlContent): unknown {
  if (typeof content === 'string') return content.replaceAll(noCharacter, '\uFFFD')
  if (Array.isArray(content)) return content.map(withoutUnknownCharacters)
  return Object.fromEntries(
    Object.entries(content ?? {}).flatMap(([name, one]) =>
      one === undefined ? [] : [[name, withoutUnknownCharacters(one)]],
    ),
  )
}
