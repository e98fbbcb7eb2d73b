/** Longest address of a board, characters. */
export const longestAddress = 4000

const partsOfTheWall = ['meeting', 'board', 'frozen']

/**
 * What is wrong with the address of a board, as a sentence; null: nothing. It is the query part of an address of this
 * page, without `?`: names and values, of the board's own site, or of none, as in a folder that is copied for another site.
 * So it can lead nowhere but into the page itself.
 */
export function addressFault(address: string, site: string): string | null {
  if (address.length > longestAddress)
    return `The address has ${address.length} characters; at most ${longestAddress} are taken. Put a simpler view on the board.`
  const parts = address.split('&').map((part) => /^([a-z][a-zA-Z-]{0,39})=([^=&#?<>"'\\\s]*)$/.exec(part))
  const named = parts.map((part) => (part ? { name: part[1] ?? '', value: decoded(part[2] ?? '') } : null))
  if (named.some((part) => part === null || part.value === null))
    return `"${shortened(address)}" is not the query part of an address of this page. Open the view that is to be shown and put it on the board from there.`
  const sites = named.flatMap((part) => (part?.name === 'site' ? part.value : []))
  if (sites.length > 1 || (sites.length === 1 && sites[0] !== site))
    return `The address is not of this site. It may say site=${site} once, or no site: a board shows no other.`
  const own = named.find((part) => part && partsOfTheWall.includes(part.name))
  if (own)
    return `The address says ${own.name}, which the meeting itself adds. Leave that part out of the board's address.`
  return null
}

const shortened = (text: string): string => (text.length > 60 ? `${text.slice(0, 60)} …` : text)

/** A value with its percent signs and pluses read; null: it cannot be, or holds a control character. */
function decoded(value: string): string | null {
  try {
    const text = decodeURIComponent(value.replaceAll('+', ' '))
    return [...text].some((character) => character < ' ' || character === '\u007f') ? null : text
  } catch {
    return null
  }
}
