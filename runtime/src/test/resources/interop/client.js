// A client on jsmodbus: every table and type of the project beside it. client.js PORT VECTORS
const assert = require('assert')
const fs = require('fs')
const net = require('net')
const modbus = require('jsmodbus')

const socket = new net.Socket()
const client = new modbus.client.TCP(socket, 7, 5000)
const words = buffer => Array.from({ length: buffer.length / 2 }, (_, i) => buffer.readUInt16BE(2 * i))
const body = answer => answer.response.body

async function refused (promise, code) {
  await assert.rejects(promise, error => body(error).code === code)
}

async function all () {
  for (const line of fs.readFileSync(process.argv[3], 'ascii').trim().split('\n')) {
    const [type, address, ...hex] = line.split(' ')
    const values = hex.map(word => parseInt(word, 16))
    await client.writeMultipleRegisters(+address, values)
    const holding = await client.readHoldingRegisters(+address, values.length)
    assert.deepStrictEqual(words(body(holding).valuesAsBuffer), values, type)
    const input = await client.readInputRegisters(+address, values.length)
    assert.deepStrictEqual(words(body(input).valuesAsBuffer), values, type)
  }
  const pattern = [1, 0, 1, 1, 0, 0, 1, 1, 1, 0]
  await client.writeMultipleCoils(0, pattern)
  assert.deepStrictEqual(body(await client.readCoils(0, 10)).valuesAsArray.slice(0, 10), pattern)
  await client.writeSingleCoil(1, true)
  pattern[1] = 1
  const inputs = await client.readDiscreteInputs(0, 10)
  assert.deepStrictEqual(body(inputs).valuesAsArray.slice(0, 10), pattern)
  await client.writeSingleRegister(4, 0x4711)
  assert.strictEqual(body(await client.readHoldingRegisters(4, 1)).valuesAsArray[0], 0x4711)

  // several requests in flight on one connection
  const many = []
  for (let i = 0; i < 16; i++) {
    many.push(client.writeSingleRegister(4, i).then(() => i))
  }
  assert.deepStrictEqual(await Promise.all(many), [...many.keys()])

  await refused(client.readHoldingRegisters(90, 1), 2)
  await refused(client.writeSingleRegister(3, 256), 4)
  await refused(client.writeSingleRegister(6, 1), 2)
}

socket.on('connect', () => {
  all().then(
    () => { console.log('all good'); socket.end() },
    error => { console.error(error); process.exit(1) })
})
socket.connect({ host: '127.0.0.1', port: +process.argv[2] })
