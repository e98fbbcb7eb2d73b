import { createMemo } from 'solid-js'
import type { SandboxChange } from '#domain/what-if/sandbox-change.ts'
import { readSandbox, writeSandbox } from '#domain/what-if/sandbox-text.ts'
import { whatIfText, writeWhatIf } from '../../state/what-if.ts'

const firstDays = 60

/** How far back one may look. */
export const daysToLookBack = [30, 60, 90, 180, 365] as const

/** What is tried and how far back it is looked, as the address has it, and how both are changed. */
export function createTriedChanges() {
  const parts = createMemo(() => {
    const [days = '', ...changes] = whatIfText().split(';')
    const found = daysToLookBack.find((one) => `${one}d` === days)
    return { days: found ?? firstDays, changes: readSandbox(changes.join(';')) }
  })
  const write = (days: number, changes: readonly SandboxChange[]) =>
    writeWhatIf(changes.length === 0 && days === firstDays ? '' : `${days}d;${writeSandbox(changes)}`)
  return {
    days: () => parts().days,
    changes: () => parts().changes,
    lookBack: (days: number) => write(days, parts().changes),
    tryChanges: (changes: readonly SandboxChange[]) => {
      performance.mark('what-if-asked')
      write(parts().days, changes)
    },
  }
}
