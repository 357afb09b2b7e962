package schema

// In returns a reference to a definition of the same document.
func In(name string) *Node { return &Node{Ref: "#/$defs/" + name} }

// Never returns a schema that takes nothing.
func Never() *Node { return &Node{Never: true} }

// Words takes one of the words.
func Words[T ~string](words ...T) *Node {
	n := &Node{}
	for _, w := range words {
		n.Enum = append(n.Enum, string(w))
	}
	return n
}

// Numbers takes one of the numbers.
func Numbers(numbers ...int) *Node {
	n := &Node{}
	for _, x := range numbers {
		n.Enum = append(n.Enum, x)
	}
	return n
}

// Is takes that word and nothing else.
func Is[T ~string](word T) *Node { return &Node{Const: string(word)} }

// Text takes texts of at most so many characters that the pattern matches, from
// end to end; "" is any pattern, and 0 any length.
func Text(pattern string, most int) *Node {
	n := &Node{}
	if pattern != "" {
		n.Pattern = "^(?:" + pattern + ")$"
	}
	if most > 0 {
		n.MaxLength = &most
	}
	return n
}

// From takes whole numbers from low on.
func From(low int) *Node { return &Node{Minimum: &low} }

// Between takes whole numbers from low to high.
func Between(low, high int) *Node { return &Node{Minimum: &low, Maximum: &high} }

// Each takes lists of so many items, each as n says; most 0 is any number.
func Each(n *Node, least, most int) *Node {
	out := &Node{Items: n}
	if least > 0 {
		out.MinItems = &least
	}
	if most > 0 {
		out.MaxItems = &most
	}
	return out
}

// Apart takes lists in which nothing comes twice.
func (n *Node) Apart() *Node {
	out := *n
	out.UniqueItems = true
	return &out
}

// Needs takes objects that have the fields.
func Needs(names ...string) *Node { return &Node{Required: names} }

// Field says of a field too how it is where it is not missing.
func (n *Node) Field(name string, is *Node) *Node {
	out := *n
	out.Properties = append(out.Properties[:len(out.Properties):len(out.Properties)], Property{name, is})
	return &out
}

// Filled takes texts that are not empty, Empty the empty text; both take what is
// no text.
func Filled() *Node { one := 1; return &Node{MinLength: &one} }

// Empty takes the empty text: see Filled.
func Empty() *Node { none := 0; return &Node{MaxLength: &none} }

// Field takes objects whose field is as n says, or missing.
func Field(name string, n *Node) *Node { return (&Node{}).Field(name, n) }

// Needed takes objects that have the field, which is as n says.
func Needed(name string, n *Node) *Node { return Needs(name).Field(name, n) }

// When takes what is not as cond says, and what is and is as then says too.
func When(cond, then *Node) *Node { return &Node{If: cond, Then: then} }
