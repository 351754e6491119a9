// What a refusal says: the sentence of its first fault, else of the whole.

export async function problem(answer) {
  try {
    return { type: "", ...(await answer.clone().json()) };
  } catch {
    return { type: "", detail: "The server can't take it as it is." };
  }
}

export const sentence = (told) => (told.errors && told.errors[0] ? told.errors[0].words : told.detail) || "It was refused.";
