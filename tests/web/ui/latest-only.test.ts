import { expect, it } from 'vitest'
import { latestOnly } from '../../../web/ui/latest-only.ts'

it('lets only the last of several calls answer, in whatever order they end', async () => {
  const ends = new Map<number, { resolve: (value: string) => void; reject: (cause: unknown) => void }>()
  const signals: AbortSignal[] = []
  const ask = latestOnly((arg: number, signal) => {
    signals.push(signal)
    return new Promise<string>((resolve, reject) => ends.set(arg, { resolve, reject }))
  })
  const [first, second, third] = [ask(1), ask(2), ask(3)]
  ends.get(3)?.resolve('three')
  ends.get(2)?.reject(new Error('two failed late'))
  ends.get(1)?.resolve('one')
  expect(await Promise.all([first, second, third])).toEqual([undefined, undefined, 'three'])
  expect(signals.map((signal) => signal.aborted)).toEqual([true, true, false])
})

it('hands on the failure of the call that counts', async () => {
  const ask = latestOnly(async (_: number) => {
    throw new Error('the world failed')
  })
  await expect(ask(1)).rejects.toThrow('the world failed')
})
