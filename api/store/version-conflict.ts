/** Someone else saved a version in between, or a version was left out. */
export class VersionConflict extends Error {
  readonly code = 'version-conflict'

  constructor(what: string, given: number, expected: number) {
    super(
      `${what}: version ${given} was given, but the next is ${expected}. Load the latest version and change that.`,
    )
    this.name = 'VersionConflict'
  }
}
