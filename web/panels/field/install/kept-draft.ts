import type { InstallationBody } from '#domain/field/field-bodies.ts'

/** A grid and its names are a site's own: what was typed at one must not appear at another. */
const placeOf = (site: string) => `stillground-draft installation ${site}`

/** What was being typed at a site when the page was closed; null: nothing, or not to be read. */
export function keptDraft(site: string): InstallationBody | null {
  try {
    const kept = JSON.parse(localStorage.getItem(placeOf(site)) ?? 'null') as InstallationBody | null
    return kept?.kind === 'installation' ? kept : null
  } catch {
    return null
  }
}

export function keepDraft(site: string, body: InstallationBody): void {
  try {
    localStorage.setItem(placeOf(site), JSON.stringify(body))
  } catch {
    // Storage may be forbidden; the draft then lasts until the page is closed.
  }
}
