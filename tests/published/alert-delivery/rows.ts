import type { PublishedRow } from '../published-row.ts'

const scheme = 'Standard Webhooks 1.0.0, github.com/standard-webhooks/standard-webhooks, Apache License 2.0'

/** What travels with an alert, each with where it comes from. */
export const alertDeliveryRows: readonly PublishedRow[] = [
  {
    id: 'AD-01',
    quantity: 'signature v1 (HMAC-SHA256) of a message',
    unit: '',
    kind: 'published',
    source: `${scheme}, libraries/javascript/src/webhook.test.ts, "sign function works" (the same in every library of it)`,
    inputs: {
      secret: 'whsec_MfKQ9r8GKYqrTwjUPD8ILPZIo2LaLaSw',
      id: 'msg_p5jXN8AQM9LWM0D4loKWxJek',
      atEpochSeconds: 1614265330,
      body: '{"test": 2432232314}',
    },
    expected: 'v1,g0hM9SsE+OTPJTGt/tmIKtSyZlE3uFJELVlNIOLJ1OE=',
    tolerance: 0,
  },
  {
    id: 'AD-02',
    quantity: 'signature v1a (ed25519) of a message',
    unit: '',
    kind: 'published',
    source: `${scheme}, libraries/go/webhook_asymmetric_test.go, TestAsymmetricWebhookSign`,
    inputs: {
      secret: 'whsk_VEVTVFNJR05JTkdLRVlET05PVFVTRVRISVNGT1JBTlk=',
      id: 'msg_p5jXN8AQM9LWM0D4loKWxJek',
      atEpochSeconds: 1614265330,
      body: '{"test": 2432232314}',
    },
    expected: 'v1a,tQ9V2XOqn7jL/DQenEFpqIugdBVtiMmER5mhSkXBNwM0mkATuDe6KYYUuxqtaiHeYGb7KaaBRdM5WqyeFiL8Ag==',
    tolerance: 0,
  },
  {
    id: 'AD-03',
    quantity: 'message that a device reads out of an encrypted push',
    unit: '',
    kind: 'published',
    source: 'RFC 8291, section 5 and appendix A',
    note: 'checks the reading side, with which the tests open what the project sends',
    inputs: {
      privateKey: 'q1dXpw3UpT5VOmu_cf_v6ih07Aems3njxI-JWgLcM94',
      auth: 'BTBZMqHH6r4Tts7J_aSIgg',
      body: 'DGv6ra1nlYgDCS1FRnbzlwAAEABBBP4z9KsN6nGRTbVYI_c7VJSPQTBtkgcy27mlmlMoZIIgDll6e3vCYLocInmYWAmS6TlzAC8wEqKK6PBru3jl7A_yl95bQpu6cVPTpK4Mqgkf1CXztLVBSt2Ks3oZwbuwXPXLWyouBWLVWGNWQexSgSxsj_Qulcy4a-fN',
    },
    expected: 'When I grow up, I want to be a watermelon',
    tolerance: 0,
  },
]
