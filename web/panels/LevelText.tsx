import { Show } from 'solid-js'
import { levelWords } from '#domain/levels/level-words.ts'
import type { TriggerLevel } from '#domain/site/tables.ts'
import { formatInstant } from '../ui/format-instant.ts'

/** When a level is reached and when it is left, in words. */
export function LevelText(props: { level: TriggerLevel; unit: string; zone: string }) {
  const words = () => levelWords(props.level, props.unit, (at) => formatInstant(at, props.zone))
  return (
    <>
      {words().reached}
      <Show when={words().left}>{(left) => <>; {left()}</>}</Show>
    </>
  )
}
