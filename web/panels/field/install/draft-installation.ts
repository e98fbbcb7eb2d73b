import type { InstallationBody } from '#domain/field/field-bodies.ts'

/** A draft of this form as it was kept; null: none, or not to be read. */
export function installationOf(text: string): InstallationBody | null {
  try {
    const kept = JSON.parse(text) as InstallationBody | null
    return kept?.kind === 'installation' ? kept : null
  } catch {
    return null
  }
}
