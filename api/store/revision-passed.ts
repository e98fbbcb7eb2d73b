/** Readings or records of a site changed since the revision that something was worked out by. */
export class RevisionPassed extends Error {
  override name = 'RevisionPassed'

  constructor(site: string, workedOutBy: number, now: number) {
    super(`${site} is at revision ${now}, and this was worked out by revision ${workedOutBy}`)
  }
}
