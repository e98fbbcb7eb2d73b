/** The data file is open elsewhere: one process at a time may hold it. */
export class StoreInUse extends Error {
  readonly code = 'store-in-use'
  readonly file: string

  constructor(file: string, holder: string, cause?: unknown) {
    super(
      `The data file ${file} is in use by ${holder}. Stop that one first, or start this one with another data folder.`,
      { cause },
    )
    this.name = 'StoreInUse'
    this.file = file
  }
}
