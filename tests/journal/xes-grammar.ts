/**
 * What the schema that goes with IEEE 1849 asks of a log, said again in RELAX NG and in our own words. Source: a reprint of the schema
 * (seen): elements in a fixed order and in no namespace, the version a decimal, names of extensions and classifiers without colons or
 * spaces, attributes with a key that is an XML name. Stricter than it in two things that the standard's text asks for: globals only for
 * "trace" and "event", and both keys of a classifier given.
 */
export const xesGrammar = `<?xml version="1.0"?>
<grammar xmlns="http://relaxng.org/ns/structure/1.0" datatypeLibrary="http://www.w3.org/2001/XMLSchema-datatypes">
  <start>
    <element name="log">
      <attribute name="xes.version"><data type="decimal"/></attribute>
      <attribute name="xes.features"><data type="token"/></attribute>
      <zeroOrMore>
        <element name="extension">
          <attribute name="name"><data type="NCName"/></attribute>
          <attribute name="prefix"><data type="NCName"/></attribute>
          <attribute name="uri"><data type="anyURI"/></attribute>
        </element>
      </zeroOrMore>
      <zeroOrMore>
        <element name="global">
          <attribute name="scope"><choice><value>trace</value><value>event</value></choice></attribute>
          <ref name="attributes"/>
        </element>
      </zeroOrMore>
      <zeroOrMore>
        <element name="classifier">
          <attribute name="name"><data type="NCName"/></attribute>
          <attribute name="scope"><choice><value>trace</value><value>event</value></choice></attribute>
          <attribute name="keys"><data type="token"/></attribute>
        </element>
      </zeroOrMore>
      <ref name="attributes"/>
      <zeroOrMore>
        <element name="trace">
          <ref name="attributes"/>
          <zeroOrMore>
            <element name="event"><ref name="attributes"/></element>
          </zeroOrMore>
        </element>
      </zeroOrMore>
    </element>
  </start>
  <define name="attributes">
    <zeroOrMore>
      <choice>
        <element name="string"><ref name="key"/><attribute name="value"><data type="string"/></attribute></element>
        <element name="date"><ref name="key"/><attribute name="value"><data type="dateTime"/></attribute></element>
        <element name="int"><ref name="key"/><attribute name="value"><data type="long"/></attribute></element>
        <element name="float"><ref name="key"/><attribute name="value"><data type="double"/></attribute></element>
        <element name="boolean"><ref name="key"/><attribute name="value"><data type="boolean"/></attribute></element>
      </choice>
    </zeroOrMore>
  </define>
  <define name="key">
    <attribute name="key"><data type="Name"/></attribute>
  </define>
</grammar>`;
