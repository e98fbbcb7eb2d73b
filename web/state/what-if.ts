import { createSignal } from 'solid-js'

const [whatIfText, setWhatIfText] = createSignal('')

/** The sandbox as the address carries it: how far back it looks and what is tried; empty: nothing. */
export { whatIfText }

export function writeWhatIf(text: string): void {
  setWhatIfText(text)
}
