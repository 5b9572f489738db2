"""The leaf for the crew: people, benches and hours, and the plan that follows from them."""
