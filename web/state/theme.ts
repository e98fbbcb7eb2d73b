import { createMemo, createRoot, createSignal } from 'solid-js'
import { onPrinting } from '../ui/on-printing.ts'
import { type Palette, palettes } from '../ui/palettes.ts'
import { isOnWall } from './on-wall.ts'

/** Paper is light, room is dark, sun has the most contrast; `as-device` follows the device's own setting. */
export type ThemeChoice = 'as-device' | 'paper' | 'room' | 'sun'

const key = 'stillground-theme'
const dark = globalThis.matchMedia?.('(prefers-color-scheme: dark)')

const [themeChoice, setThemeChoice] = createSignal<ThemeChoice>(readChoice())
const [deviceDark, setDeviceDark] = createSignal(dark?.matches ?? false)
dark?.addEventListener('change', (event) => setDeviceDark(event.matches))
const [printing, setPrinting] = createSignal(false)
onPrinting(setPrinting)

export { themeChoice }

/** What a meeting is held in: its boards have more contrast than a sheet at a desk. */
export const rooms = ['light', 'dark'] as const
export type Room = (typeof rooms)[number]

const roomKey = 'stillground-room'
const [roomChoice, setRoomChoice] = createSignal<Room | null>(readRoom())

/** Whether the room of the meeting is light or dark; as the device is, until somebody chose. */
export const room = (): Room => roomChoice() ?? (deviceDark() ? 'dark' : 'light')

/** Chooses it and remembers it on this device. */
export function chooseRoom(chosen: Room): void {
  setRoomChoice(chosen)
  try {
    localStorage.setItem(roomKey, chosen)
  } catch {
    // Storage may be forbidden; the choice then lasts until the page is closed.
  }
}

/** The theme that is drawn. On paper it is always the light one. */
export const theme = (): Exclude<ThemeChoice, 'as-device'> => {
  if (printing()) return 'paper'
  if (isOnWall()) return room() === 'dark' ? 'room' : 'paper'
  const choice = themeChoice()
  if (choice !== 'as-device') return choice
  return deviceDark() ? 'room' : 'paper'
}

/** Colours of the theme that is drawn; views take them from here. */
export const palette = createRoot(() =>
  createMemo((): Palette => {
    if (isOnWall() && !printing()) return palettes[room() === 'dark' ? 'darkRoom' : 'lightRoom']
    return palettes[theme()]
  }),
)

/** Chooses a theme and remembers it on this device. */
export function chooseTheme(choice: ThemeChoice): void {
  setThemeChoice(choice)
  try {
    localStorage.setItem(key, choice)
  } catch {
    // Storage may be forbidden; the choice then lasts until the page is closed.
  }
}

function readRoom(): Room | null {
  try {
    return rooms.find((one) => one === localStorage.getItem(roomKey)) ?? null
  } catch {
    return null
  }
}

function readChoice(): ThemeChoice {
  try {
    const kept = localStorage.getItem(key)
    return kept === 'paper' || kept === 'room' || kept === 'sun' ? kept : 'as-device'
  } catch {
    return 'as-device'
  }
}
