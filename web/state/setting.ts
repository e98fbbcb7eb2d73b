import { createSignal } from 'solid-js'

/** Where the page is used: at the desk, on a wall in a meeting, or walking the works with a tablet. */
export const settings = ['desk', 'wall', 'walk'] as const
export type Setting = (typeof settings)[number]

const key = 'stillground-setting'
const [setting, setSetting] = createSignal<Setting>(readSetting())

export { setting }

/** Chooses the setting and remembers it on this device. */
export function chooseSetting(chosen: Setting): void {
  setSetting(chosen)
  try {
    localStorage.setItem(key, chosen)
  } catch {
    // Storage may be forbidden; the choice then lasts until the page is closed.
  }
}

function readSetting(): Setting {
  try {
    return settings.find((one) => one === localStorage.getItem(key)) ?? 'desk'
  } catch {
    return 'desk'
  }
}
