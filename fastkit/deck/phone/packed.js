/* What the page carries, unpacked when it is first asked for. */

const unpacked = new Map();

function carried(name) {
  if (!unpacked.has(name)) unpacked.set(name, unpack(name));
  return unpacked.get(name);
}

async function unpack(name) {
  if (typeof DecompressionStream === "undefined") {
    trouble("This reader is too old to unpack what the page carries; its cards can be read.");
    return null;
  }
  const bytes = Uint8Array.from(atob(one(`#data-${name}`).textContent), (c) => c.charCodeAt(0));
  const stream = new Blob([bytes]).stream().pipeThrough(new DecompressionStream("gzip"));
  return JSON.parse(await new Response(stream).text());
}
