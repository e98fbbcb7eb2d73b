/** Writes what whoever runs the server must know, each with its instant in UTC (RFC 3339). */
export const createReport =
  (now: () => number, write: (line: string) => void) =>
  (line: string): void =>
    write(`${new Date(now()).toISOString()} ${line}`)
