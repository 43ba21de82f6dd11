"""The registers that a nursery keeps: treatments, plants in and out, stock, unpaid bills."""
