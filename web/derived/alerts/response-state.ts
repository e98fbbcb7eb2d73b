import type { ListedAlert } from '#contract/alerts.ts'
import { isStillReached } from '#domain/alerts/alert.ts'

/** How far people are with an alert: whether it was handed over to somebody does not matter until somebody took it up. */
export const responseStates = ['nobody', 'taken-up', 'verified', 'closed'] as const
export type ResponseState = (typeof responseStates)[number]

export const responseOf = ({ state }: Pick<ListedAlert, 'state'>): ResponseState =>
  state === 'raised' || state === 'delivered' ? 'nobody' : state === 'acknowledged' ? 'taken-up' : state

export const isOpen = ({ closed }: Pick<ListedAlert, 'closed'>): boolean => closed === null

/** Level number of an alert; 0 for a drill. */
export const levelOfAlert = ({ cause }: Pick<ListedAlert, 'cause'>): number =>
  cause.kind === 'level' ? cause.level.level : 0

/** Since when what is told of has been so: when the level was reached; of a drill, when it was raised. */
export const sinceEpochMs = ({
  episode,
  raisedAtEpochMs,
}: Pick<ListedAlert, 'episode' | 'raisedAtEpochMs'>) => episode?.crossedAtEpochMs ?? raisedAtEpochMs

/** Whether the level is still reached; null where the alert is no longer borne out, or is a drill. */
export const stillReached = (alert: ListedAlert): boolean | null =>
  alert.episode === null || !alert.bornOut
    ? null
    : isStillReached({ ...alert, attempts: alert.attempts ?? [] })
