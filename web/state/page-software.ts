/**
 * Version of the program that this page was built from, which need not be the server's: a device keeps pages.
 * Null: it was not built but is served as it is written, so the server's is its own.
 */
export const pageSoftware = (): string | null =>
  (import.meta.env?.VITE_SOFTWARE as string | undefined) ?? null
