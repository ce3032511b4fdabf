// Lets discs fall between two pins, or into a vee, in a world with gravity, by a general-purpose 2D physics library, and says
// where they come to rest: an independent way to find a seat.
// Usage: node drop_discs.js NEST RADIUS…; NEST is {"spacing":…,"diameter":…} of two pins, or {"angle":…} of a vee, and all
// lengths are in metres, angles in degrees. Prints one JSON object: rest, [across, along the seat axis] of each disc, metres.
"use strict";
const path = require("node:path");
const { createRequire } = require("node:module");

const need = createRequire(path.join(__dirname, "..", "..", "node", "package.json"));
const planck = need("planck");

// The library is made for things of 0.1 to 10 units; its slop is 0.005 units, which is 0.05 mm here.
const SCALE = 100, STEPS = 4000, STEP = 1 / 240;

function rest(nest, radius) {
  const world = new planck.World({ gravity: { x: 0, y: -10 }, allowSleep: false });
  const ground = world.createBody();
  if (nest.angle === undefined) {
    for (const side of [-1, 1]) ground.createFixture({ shape: new planck.Circle({ x: (side * nest.spacing * SCALE) / 2, y: 0 }, (nest.diameter * SCALE) / 2), friction: 0 });
  } else {
    const half = ((nest.angle / 2) * Math.PI) / 180;
    for (const side of [-1, 1]) ground.createFixture({ shape: new planck.Edge({ x: 0, y: 0 }, { x: side * 40 * Math.sin(half), y: 40 * Math.cos(half) }), friction: 0 });
  }

  // Dropped beside the middle, so that it has to find its seat.
  const disc = world.createBody({ type: "dynamic", position: { x: 0.1 * radius * SCALE, y: 3 * radius * SCALE + 5 }, linearDamping: 1.5, bullet: true });
  disc.createFixture({ shape: new planck.Circle(radius * SCALE), density: 1, friction: 0, restitution: 0 });
  for (let i = 0; i < STEPS; i++) world.step(STEP, 20, 20);
  const at = disc.getPosition();
  return [at.x / SCALE, at.y / SCALE];
}

const [nest, ...radii] = process.argv.slice(2).map(a => JSON.parse(a));
console.log(JSON.stringify({ rest: radii.map(r => rest(nest, r)) }));
