/** A number of bytes as people say it. */
export function sizeText(bytes: number): string {
  return bytes >= 1024 ** 3
    ? `${Number((bytes / 1024 ** 3).toFixed(1))} GiB`
    : `${Number((bytes / 1024 ** 2).toFixed(1))} MiB`
}
