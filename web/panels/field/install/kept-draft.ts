import type { InstallationBody } from '#domain/field/field-bodies.ts'

const place = 'stillground-installation-draft'

/** What was being typed when the page was closed; null: nothing, or not to be read. */
export function keptDraft(): InstallationBody | null {
  try {
    const kept = JSON.parse(localStorage.getItem(place) ?? 'null') as InstallationBody | null
    return kept?.kind === 'installation' ? kept : null
  } catch {
    return null
  }
}

export function keepDraft(body: InstallationBody): void {
  try {
    localStorage.setItem(place, JSON.stringify(body))
  } catch {
    // Storage may be forbidden; the draft then lasts until the page is closed.
  }
}
