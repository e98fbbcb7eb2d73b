import { beforeAll, beforeEach, expect, test, vi } from 'vitest'

const shown: { title: string; options: Record<string, unknown> }[] = []
const opened: string[] = []
const sent: { path: string; body: unknown }[] = []
const subscribed: unknown[] = []

// The worker takes `self` for its scope; here that is the window, with what a worker has beside.
beforeAll(async () => {
  Object.assign(self, {
    skipWaiting: async () => undefined,
    registration: {
      showNotification: async (title: string, options: Record<string, unknown>) =>
        void shown.push({ title, options }),
      pushManager: {
        subscribe: async (options: unknown) => {
          subscribed.push(options)
          return {
            toJSON: () => ({ endpoint: 'https://push.example/new', keys: { p256dh: 'k', auth: 'a' } }),
          }
        },
      },
    },
    clients: { openWindow: async (path: string) => void opened.push(path) },
  })
  vi.stubGlobal('fetch', async (path: string, { body }: RequestInit) => {
    sent.push({ path, body: JSON.parse(String(body)) })
    return new Response(null, { status: 201 })
  })
  // By a name that types do not follow: the worker's types are those of a worker, not of a page.
  const worker = '../../../web/service-worker/push-worker.ts'
  await import(/* @vite-ignore */ worker)
})
beforeEach(() => {
  for (const list of [shown, opened, sent, subscribed]) list.length = 0
})

/** Gives the worker an event and waits for what it does with it. */
async function happens(kind: string, properties: object): Promise<void> {
  const tasks: Promise<unknown>[] = []
  self.dispatchEvent(
    Object.assign(new Event(kind), { waitUntil: (task: Promise<unknown>) => tasks.push(task) }, properties),
  )
  expect(tasks).toHaveLength(1)
  await Promise.all(tasks)
}

test('a push is shown until somebody puts it away, and heard though an earlier one stands there', async () => {
  const content = { title: 'Level 2 passed', body: 'b', path: '/?site=a', tag: 'a/17', atEpochMs: 5 }
  await happens('push', { data: { text: () => JSON.stringify(content) } })
  expect(shown).toEqual([
    {
      title: 'Level 2 passed',
      options: expect.objectContaining({
        body: 'b',
        tag: 'a/17',
        renotify: true,
        requireInteraction: true,
        timestamp: 5,
        data: { path: '/?site=a' },
      }),
    },
  ])
})

test('a push without content shows something all the same', async () => {
  await happens('push', { data: null })
  expect(shown[0]?.title).toBe('Something is to be looked at')
})

test('pressing it opens its address in the page, and no other server', async () => {
  const press = (path: unknown) =>
    happens('notificationclick', { notification: { close: () => undefined, data: { path } } })
  await press('/?site=a')
  await press('https://elsewhere.example/')
  await press(undefined)
  expect(opened).toEqual(['/?site=a', '/', '/'])
})

test('an address that the browser replaced is told to the server', async () => {
  const options = { userVisibleOnly: true }
  await happens('pushsubscriptionchange', { oldSubscription: { options }, newSubscription: null })
  expect(subscribed).toEqual([options])
  expect(sent).toEqual([
    {
      path: '/api/me/devices',
      body: { endpoint: 'https://push.example/new', keys: { p256dh: 'k', auth: 'a' } },
    },
  ])
})
