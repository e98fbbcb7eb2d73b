import { expect, it } from 'vitest'
import { newestNext } from '../../../web/ui/newest-next.ts'

const soon = () => new Promise((resolve) => setTimeout(resolve, 0))

it('answers the first and the newest, one at a time, and none between', async () => {
  const answered: number[] = []
  const waiting: ((value: string) => void)[] = []
  let atOnce = 0
  let most = 0
  const ask = newestNext(
    (_: number) => {
      atOnce += 1
      most = Math.max(most, atOnce)
      return new Promise<string>((resolve) => waiting.push(resolve)).finally(() => {
        atOnce -= 1
      })
    },
    (_, arg) => answered.push(arg),
    () => answered.push(-1),
  )
  ask(1)
  ask(2)
  ask(3)
  waiting.shift()?.('')
  await soon()
  waiting.shift()?.('')
  await soon()
  expect(answered).toEqual([1, 3])
  expect(most).toBe(1)
  ask(4)
  waiting.shift()?.('')
  await soon()
  expect(answered).toEqual([1, 3, 4])
})

it('goes on after a failure', async () => {
  const heard: string[] = []
  const ask = newestNext(
    async (arg: number) => {
      if (arg === 1) throw new Error('no')
      return arg
    },
    (value) => heard.push(`got ${value}`),
    (_, arg) => heard.push(`failed ${arg}`),
  )
  ask(1)
  ask(2)
  await soon()
  expect(heard).toEqual(['failed 1', 'got 2'])
})
