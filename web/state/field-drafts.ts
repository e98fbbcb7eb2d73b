import { createSignal } from 'solid-js'

/** What is typed into a form of field work and not kept yet, by form and site. */
const texts = new Map<string, string>()
const [files, setFiles] = createSignal<ReadonlyMap<string, readonly File[]>>(new Map())

const place = (form: string) => `stillground-draft ${form}`

/** Text of a draft: outlives another page being opened, and the page being closed. Empty: none. */
export function draftText(form: string): string {
  try {
    return localStorage.getItem(place(form)) ?? texts.get(form) ?? ''
  } catch {
    return texts.get(form) ?? ''
  }
}

export function keepDraftText(form: string, text: string): void {
  texts.set(form, text)
  try {
    if (text === '') localStorage.removeItem(place(form))
    else localStorage.setItem(place(form), text)
  } catch {
    // Storage may be full or forbidden; the draft then lasts until the page is closed.
  }
}

/** Photos and files of a draft: they outlive another page being opened, not the page being closed. */
export const draftFiles = (form: string): readonly File[] => files().get(form) ?? []

export const keepDraftFiles = (form: string, chosen: readonly File[]): void => {
  setFiles((now) => new Map([...now, [form, chosen]]))
}

/** Whether closing the page would lose a photo or file that was added and not kept yet. */
export const hasUnkeptFiles = (): boolean => [...files().values()].some((chosen) => chosen.length > 0)
