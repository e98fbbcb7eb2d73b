/** A value from outside the project, and where it comes from. */
export interface PublishedRow {
  readonly id: string
  readonly quantity: string
  readonly kind: 'published' | 'reference software' | 'common practice, no published source' | 'from memory'
  readonly source: string
  readonly inputs: Readonly<Record<string, unknown>>
  readonly expected: unknown
  readonly tolerance: unknown
}
