const place = 'own-name'

/** The name that this device's user last signed a change with; empty at first, or where nothing may be kept. */
export function rememberedName(): string {
  try {
    return localStorage.getItem(place) ?? ''
  } catch {
    return ''
  }
}

export function rememberName(name: string): void {
  try {
    localStorage.setItem(place, name.trim())
  } catch {
    // A device that keeps nothing asks again.
  }
}
