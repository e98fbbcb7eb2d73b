import type { Issue } from '#domain/outcome.ts'

/** One text replaced in one file of the small site, and the fault that must be told. */
export type FolderFault = [file: string, from: string, to: string, expected: Partial<Issue>, says: RegExp]
