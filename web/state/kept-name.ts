const place = 'own-name'

/** A name kept on this device; empty: none. */
export function keptName(): string {
  try {
    return localStorage.getItem(place) ?? ''
  } catch {
    return ''
  }
}

export function keepName(name: string): void {
  try {
    localStorage.setItem(place, name.trim())
  } catch {
    // A device that keeps nothing asks again.
  }
}

export function forgetName(): void {
  try {
    localStorage.removeItem(place)
  } catch {
    // Nothing was kept.
  }
}
