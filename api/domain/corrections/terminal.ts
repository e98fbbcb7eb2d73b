import type { Wiring } from '../site/tables.ts'
import type { Terminal } from './correction.ts'

export const isSameTerminal = (one: Terminal, other: Terminal): boolean =>
  one.logger === other.logger && one.channel === other.channel

export const terminalText = ({ logger, channel }: Terminal): string => `channel ${channel} of ${logger}`

export const endOf = ({ untilAt }: Pick<Wiring, 'untilAt'>): number => untilAt ?? Number.POSITIVE_INFINITY
