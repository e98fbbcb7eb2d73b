import { createSignal } from 'solid-js'
import type { Board } from '#domain/meeting/meeting.ts'
import { siteDocument } from './site-document.ts'

/** Boards that are being put together and not saved; `version`: which were looked at. */
export interface BoardWork {
  readonly version: number
  readonly boards: readonly Board[]
}

/** A minute that is being written. */
export interface MinuteWork {
  readonly kind: 'note' | 'action'
  readonly text: string
  readonly places: readonly string[]
  readonly owner: string
  readonly dueOn: string
}

export const emptyMinute: MinuteWork = { kind: 'action', text: '', places: [], owner: '', dueOn: '' }

const [opened, setOpened] = createSignal<{ readonly site: string; readonly meeting: number } | null>(null)
const [gathering, setGathering] = createSignal<{ readonly site: string; readonly meeting: number } | null>(
  null,
)
const [boardWork, setBoardWork] = createSignal<Readonly<Record<string, BoardWork>>>({})
const [minuteWork, setMinuteWork] = createSignal<Readonly<Record<string, MinuteWork>>>({})

const site = (): string => siteDocument()?.facts.id ?? ''
const keyOf = (meeting: number): string => `${site()} ${meeting}`

/** Meeting that is looked at in the sheet; null: their list. One that was opened before any site was is of the first. */
export const openedMeeting = (): number | null => {
  const known = opened()
  return known && (known.site === '' || known.site === site()) ? known.meeting : null
}

export function openMeeting(meeting: number | null): void {
  setOpened(meeting === null ? null : { site: site(), meeting })
}

/** Meeting onto whose boards whatever is seen may be put, from wherever one is; null: none. */
export const gatheringFor = (): number | null =>
  gathering()?.site === site() ? (gathering()?.meeting ?? null) : null

export function gatherFor(meeting: number | null): void {
  setGathering(meeting === null ? null : { site: site(), meeting })
}

/** Unsaved boards of a meeting; null: none. They stay while one looks at something else. */
export const boardWorkOf = (meeting: number): BoardWork | null => boardWork()[keyOf(meeting)] ?? null

export function workOnBoards(meeting: number, work: BoardWork | null): void {
  setBoardWork(({ [keyOf(meeting)]: _, ...others }) =>
    work === null ? others : { ...others, [keyOf(meeting)]: work },
  )
}

/** What is being written for a meeting; stays while one looks at something else, and when the server does not take it. */
export const minuteWorkOf = (meeting: number): MinuteWork => minuteWork()[keyOf(meeting)] ?? emptyMinute

export function workOnMinute(meeting: number, some: Partial<MinuteWork> | null): void {
  setMinuteWork(({ [keyOf(meeting)]: before, ...others }) =>
    some === null ? others : { ...others, [keyOf(meeting)]: { ...(before ?? emptyMinute), ...some } },
  )
}
