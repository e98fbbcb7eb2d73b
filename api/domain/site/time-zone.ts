/** Whether a text is UTC or an IANA zone name that this machine knows. Plain offsets are not zones. */
export function isTimeZone(name: string): boolean {
  if (/^[+-]/.test(name)) return false
  try {
    new Intl.DateTimeFormat('en', { timeZone: name })
    return true
  } catch {
    return false
  }
}
